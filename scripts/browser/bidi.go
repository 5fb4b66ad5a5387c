package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"sync"

	"github.com/coder/websocket"
)

// bidi is a connection that speaks WebDriver BiDi (W3C), as far as it is needed
// here: commands with their answers, and events.
type bidi struct {
	socket *websocket.Conn
	hear   func(event string, params json.RawMessage)

	mu      sync.Mutex
	next    int
	waiting map[int]chan bidiAnswer
	gone    error
}

// bidiAnswer is what comes from the browser.
type bidiAnswer struct {
	ID      int             `json:"id"`
	Type    string          `json:"type"` // success, error, event
	Result  json.RawMessage `json:"result"`
	Error   string          `json:"error"`
	Message string          `json:"message"`
	Method  string          `json:"method"` // of an event
	Params  json.RawMessage `json:"params"`
}

func dialBidi(address string, hear func(event string, params json.RawMessage)) (*bidi, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	socket, _, err := websocket.Dial(ctx, address, nil)
	if err != nil {
		return nil, err
	}
	socket.SetReadLimit(-1) // pictures are large
	b := &bidi{socket: socket, hear: hear, waiting: map[int]chan bidiAnswer{}}
	go b.listen()
	return b, nil
}

func (b *bidi) listen() {
	for {
		_, text, err := b.socket.Read(context.Background())
		var a bidiAnswer
		if err == nil {
			err = json.Unmarshal(text, &a)
		}
		if err != nil {
			b.mu.Lock()
			b.gone = fmt.Errorf("browser: the connection ended: %w", err)
			for id, answer := range b.waiting {
				delete(b.waiting, id)
				close(answer)
			}
			b.mu.Unlock()
			return
		}
		if a.Type == "event" {
			b.hear(a.Method, a.Params)
			continue
		}
		b.mu.Lock()
		answer := b.waiting[a.ID]
		delete(b.waiting, a.ID)
		b.mu.Unlock()
		if answer != nil {
			answer <- a
		}
	}
}

// call sends a command and decodes its result into out, where there is one.
func (b *bidi) call(method string, params map[string]any, out any) error {
	answer := make(chan bidiAnswer, 1)
	b.mu.Lock()
	b.next++
	id, gone := b.next, b.gone
	b.waiting[id] = answer
	b.mu.Unlock()
	if gone != nil {
		return gone
	}
	text, err := json.Marshal(map[string]any{"id": id, "method": method, "params": params})
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if err := b.socket.Write(ctx, websocket.MessageText, text); err != nil {
		return err
	}
	select {
	case a, there := <-answer:
		switch {
		case !there:
			return b.gone
		case a.Type == "error":
			return fmt.Errorf("browser: %s: %s: %s", method, a.Error, a.Message)
		case out == nil:
			return nil
		}
		return json.Unmarshal(a.Result, out)
	case <-ctx.Done():
		return fmt.Errorf("browser: %s: %w", method, ctx.Err())
	}
}

func (b *bidi) close() { _ = b.socket.CloseNow() }

// evaluate evaluates an expression in a context, as [Tab.Eval] does.
func (b *bidi) evaluate(context, js string, out any) error {
	expression := js
	if out != nil { // BiDi has a writing of values of its own
		expression = "(async () => JSON.stringify(await (\n" + js + "\n)) ?? '')()"
	}
	var r struct {
		Type             string
		Result           struct{ Value json.RawMessage }
		ExceptionDetails struct{ Text string }
	}
	err := b.call("script.evaluate", map[string]any{
		"expression": expression, "target": map[string]any{"context": context}, "awaitPromise": true,
		"serializationOptions": map[string]any{"maxDomDepth": 0, "maxObjectDepth": 0},
	}, &r)
	switch {
	case err != nil:
		return err
	case r.Type == "exception":
		return fmt.Errorf("browser: %s in %.200s", r.ExceptionDetails.Text, js)
	case out == nil:
		return nil
	}
	return decode(r.Result.Value, js, out)
}

// decode reads the value of an expression that a browser wrote as JSON, and as a text again.
func decode(quoted []byte, js string, out any) error {
	var text string
	if err := json.Unmarshal(quoted, &text); err != nil {
		return err
	}
	if text == "" {
		return noValue(js)
	}
	return json.Unmarshal([]byte(text), out)
}
